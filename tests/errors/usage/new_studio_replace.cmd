lemel new studio --replace
