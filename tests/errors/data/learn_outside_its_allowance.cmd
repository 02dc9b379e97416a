lemel run learn allowance=wastage jobs='[{ "job": "clasp", "actual": "7 %" }, { "job": "ring", "actual": "80 %" }]'
lemel run learn allowance=wastage jobs='[{ "job": "clasp", "actual": "0.7 g" }, { "job": "ring", "actual": "0.8 g" }]'
lemel run learn allowance=crucibles jobs='[{ "job": "clasp", "actual": "7 %" }, { "job": "ring", "actual": "8 %" }]'
