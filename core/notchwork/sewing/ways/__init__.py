"""Which way things lie: hands, ends exchanged, joints, and what meets at them."""
