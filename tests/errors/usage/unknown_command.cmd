lemel rum
