lemel compare cast cast jobs --within 3
