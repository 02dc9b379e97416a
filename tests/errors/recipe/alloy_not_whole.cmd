lemel reckon 'alloy { composition = { Au = "500 ‰", Ag = "400 ‰" } }'
