"""The plan with the lateral force in each solid length."""
