lemel batch jobs --workers 0
