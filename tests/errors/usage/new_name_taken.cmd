lemel new recipe pour
