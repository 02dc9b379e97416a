# The line in the recipe is not what is held fast here.
lemel run quote date=2026-11-24T10:00 finished='6.30 g' fineness='585 ‰' prices='{"Au": {"price": "90 USD/g", "at": "2026-11-24", "from": "list"}}' client_fine='5 g Ag' rates='{"bench": "65 USD/h"}' overhead='18 USD/h' premium='2 %' place=US 2>said
status=$?
sed "s/lua:[0-9]*:/lua:/" said >&2
exit $status
