lemel recipes -o none/out.txt
