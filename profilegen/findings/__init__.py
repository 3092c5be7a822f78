"""What a careful machinist would object to: findings as data, and the catalogue that words them."""
