lemel recipes --format yaml
