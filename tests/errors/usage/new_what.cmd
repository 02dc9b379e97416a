lemel new job
