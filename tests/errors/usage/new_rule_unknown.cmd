lemel new rule ours
