lemel schema
