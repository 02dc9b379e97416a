lemel
