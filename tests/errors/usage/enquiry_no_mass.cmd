lemel enquiry "9 g signet in 14kt from an 18 kt ring"
