lemel learn melt_loss jobs/none.json
