lemel units --format html
