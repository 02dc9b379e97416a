lemel units g kg
