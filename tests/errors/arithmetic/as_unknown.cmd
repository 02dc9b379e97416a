lemel reckon "1 g" as gm
