mkdir x; cd x; lemel new studio plaice=US
