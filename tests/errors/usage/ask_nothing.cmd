lemel ask
