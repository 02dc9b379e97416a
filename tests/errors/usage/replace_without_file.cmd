lemel recipes --replace
