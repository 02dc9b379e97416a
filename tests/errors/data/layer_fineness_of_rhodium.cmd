# The line in the recipe is not what is held fast here.
lemel run plate bath=rhodium area='8 cm2' current='0.2 A' efficiency='75 %' thickness='0.25 µm' cyanide_near=false layer_fineness='585 ‰' 2>said
status=$?
sed "s/lua:[0-9]*:/lua:/" said >&2
exit $status
