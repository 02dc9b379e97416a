lemel new recipe
