lemel new job cast tin; lemel new job cast tin
