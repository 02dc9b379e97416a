# A gauge shows a depth or an absolute pressure, and 25 inHg does not say which.
lemel run vacuum altitude="100 m" gauge="25 inHg"
