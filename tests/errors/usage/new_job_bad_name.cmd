lemel new job cast ../x
