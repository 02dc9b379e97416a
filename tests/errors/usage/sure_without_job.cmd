lemel sure
