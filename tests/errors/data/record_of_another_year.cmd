lemel record jobs/links.json tree mass="31 g" --at 2016-11-26T14:20
