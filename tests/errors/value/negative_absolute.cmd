lemel reckon -- '-1 bar abs'
