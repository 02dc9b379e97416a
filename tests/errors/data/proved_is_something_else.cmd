echo mine > recipes/proved.txt; lemel prove cast
