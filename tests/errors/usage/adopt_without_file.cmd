lemel adopt
