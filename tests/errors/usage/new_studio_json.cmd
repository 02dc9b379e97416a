mkdir x; cd x; lemel new studio 'rates={"bench": 60 USD/h}'
