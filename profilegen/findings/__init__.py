"""What a careful machinist would object to: what every finding means."""
