lemel reckon "1 g" --digits many
