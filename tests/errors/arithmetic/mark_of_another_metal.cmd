# The line in the recipe is not what is held fast here.
lemel run charge mass='40 g' target='751 ‰' promised='925 ‰ Ag' scale_step='0.01 g' lots='[{"name": "old", "metal": "800 ‰"}]' 2>said
status=$?
sed "s/lua:[0-9]*:/lua:/" said >&2
exit $status
