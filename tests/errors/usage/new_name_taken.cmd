lemel new recipe cast
