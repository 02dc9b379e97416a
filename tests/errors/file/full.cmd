lemel recipes > /dev/full
