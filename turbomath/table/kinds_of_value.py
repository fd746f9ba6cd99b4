"""What stands for numbers in type hints."""

import numpy as np
from numpy.typing import NDArray

Values = float | NDArray[np.float64]  # one number, or an array of them
