# The line in the recipe is not what is held fast here.
lemel run stone stones='[{"kind": "ruby", "cut": "oval", "length": "3.5 mm"}]' 2>said
status=$?
sed "s/lua:[0-9]*:/lua:/" said >&2
exit $status
