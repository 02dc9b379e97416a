lemel check
