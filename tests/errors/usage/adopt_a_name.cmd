lemel adopt cast
