# The line in the recipe is not what is held fast here.
lemel run plate bath=rhodium plain_band='{"inside": "20 mm", "outside": "18 mm", "width": "4 mm"}' current='0.2 A' efficiency='75 %' thickness='0.25 µm' cyanide_near=false 2>said
status=$?
sed "s/lua:[0-9]*:/lua:/" said >&2
exit $status
