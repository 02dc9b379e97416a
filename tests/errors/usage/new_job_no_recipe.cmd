lemel new job casst tin
