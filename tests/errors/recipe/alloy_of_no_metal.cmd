lemel reckon 'alloy { name = "hard white", composition = { Au = "500 ‰", Os = "500 ‰" } }'
