lemel batch
