# Words that are not silver, a filled shell, and old silver that may hold cadmium.
. "$(dirname "$0")/intake.sh"
pieces '[{"name": "forks", "gross": "300 g", "stamp": "EPNS", "wish": "melt"}, {"name": "ladle", "gross": "90 g", "stamp": "alpaca", "wish": "melt"}, {"name": "candlestick", "gross": "400 g", "stamp": "STERLING WEIGHTED", "wish": "melt"}, {"name": "cup", "gross": "120 g", "stamp": "835", "wish": "melt", "consent": true}]'
