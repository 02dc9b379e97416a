lemel book
