lemel batch jobs --format text
