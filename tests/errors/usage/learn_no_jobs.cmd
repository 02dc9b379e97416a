lemel learn melt_loss was="1 %"
