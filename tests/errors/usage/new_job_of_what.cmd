lemel new job cast
