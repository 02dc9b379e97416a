lemel new recipe "Old Metal"
