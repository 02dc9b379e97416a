-- want: BAD_RECIPE "'package' is not known here"
return { out = package }
