lemel new job cast tin --replace
