lemel price Au "103.40 USD/g" --at 2027-11-24T09:00 --from list
