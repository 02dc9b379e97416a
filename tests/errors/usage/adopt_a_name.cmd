lemel adopt pour
