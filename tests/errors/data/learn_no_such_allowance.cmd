lemel run learn allowance=wastge jobs='[{ "job": "clasp", "actual": "7 %" }, { "job": "ring", "actual": "8 %" }]'
lemel run learn allowance=need.skul jobs='[{ "job": "clasp", "actual": "0.3 g" }, { "job": "ring", "actual": "0.4 g" }]'
lemel run learn allowance=needs.skull jobs='[{ "job": "clasp", "actual": "0.3 g" }, { "job": "ring", "actual": "0.4 g" }]'
