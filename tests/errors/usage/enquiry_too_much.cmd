lemel enquiry "6 g" 14kt "9 g" 18kt
