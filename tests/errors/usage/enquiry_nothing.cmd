lemel enquiry
