lemel again
