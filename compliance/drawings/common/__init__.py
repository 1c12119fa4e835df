"""What every drawing is made with: primitives, scales, lettering, placing, dimension chains."""
