"""What a finding becomes by something beside its rule: the types of earth its rule set covers, an official's word."""
