-- want: BAD_RECIPE
return { out = craft.element("Au\0Ag").density }
