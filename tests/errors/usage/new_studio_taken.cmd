lemel new studio
