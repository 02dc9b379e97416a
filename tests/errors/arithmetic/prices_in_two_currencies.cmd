# The line in the recipe is not what is held fast here.
lemel run charge mass='40 g' target='751 ‰' scale_step='0.01 g' lots='[{"name": "old", "metal": "585 ‰", "price": "50 USD/g"}, {"name": "fine", "metal": "999.9 ‰", "price": "95 EUR/g"}]' 2>said
status=$?
sed "s/lua:[0-9]*:/lua:/" said >&2
exit $status
