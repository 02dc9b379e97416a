lemel new recipe polish --replace
