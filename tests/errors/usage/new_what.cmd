lemel new house
