lemel reckon 'Q"1 bar abs" * -1'
