-- want: BAD_RECIPE "'_G' is not known here"
return { out = _G }
