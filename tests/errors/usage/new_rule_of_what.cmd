lemel new rule
