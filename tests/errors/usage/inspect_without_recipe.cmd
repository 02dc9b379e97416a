lemel inspect
