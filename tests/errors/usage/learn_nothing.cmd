lemel learn
