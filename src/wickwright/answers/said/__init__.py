"""What callers say: wishes, complaints, breakages, numbers and kinds in their own words."""
