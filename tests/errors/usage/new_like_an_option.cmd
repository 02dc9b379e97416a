lemel new recipe -- --help
