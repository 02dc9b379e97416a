lemel recipes --rules wather
