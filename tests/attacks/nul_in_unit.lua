-- want: BAD_RECIPE
return { out = Q("5 g"):as "ct\0 or g" }
