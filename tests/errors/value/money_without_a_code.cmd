for amount in "95 kr" "950 kr/g" "3 euros" "4 dollars"; do lemel reckon "$amount"; done
