lemel enquiry "6 g" 14kt from
