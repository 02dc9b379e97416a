lemel recipes all
