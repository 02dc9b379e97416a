lemel compare pour pour jobs --within "3 furlong"
