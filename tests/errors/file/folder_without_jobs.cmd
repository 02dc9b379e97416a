mkdir empty && lemel batch empty
