# The line in the recipe is not what is held fast here.
lemel run plate bath='gold, sulfite' area='8 cm2' current='0.02 A' efficiency='95 %' thickness='0.25 µm' acid_near=false tank='{"volume": "500 mL", "strength": "8 g/L", "floor": "4 g/L", "concentrate": "8 g/L"}' 2>said
status=$?
sed "s/lua:[0-9]*:/lua:/" said >&2
exit $status
