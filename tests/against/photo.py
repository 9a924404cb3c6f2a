"""The angle between the two families of threads in pictures of braids, by the structure tensor of scikit-image.

Run by hand: pip install numpy scikit-image pillow; cargo test --test photo; python tests/against/photo.py target/photo-pictures
It prints the figures of tests/photo/library.rs. It is given where the braid lies, and finds all else itself.
"""
import csv
import pathlib
import sys

import numpy
import skimage
from PIL import Image
from scipy import ndimage
from skimage.feature import structure_tensor


def laid_flat(picture, row):
    """The middle half of the round surface, rolled out on the outer diameter; columns run along the axis."""
    point = numpy.array([float(row["x"]), float(row["y"])])
    along = numpy.array([float(row["right"]), float(row["down"])])
    across = numpy.array([-along[1], along[0]])
    radius = float(row["diameter"]) / 2
    reach = radius * numpy.arcsin(1 / 2)
    arc = numpy.arange(-reach, reach + 0.5)
    length = numpy.arange(-260.0, 260.5)
    beside = radius * numpy.sin(arc / radius)
    x = point[0] + length[None, :] * along[0] + beside[:, None] * across[0] - 0.5
    y = point[1] + length[None, :] * along[1] + beside[:, None] * across[1] - 0.5
    return ndimage.map_coordinates(picture, [y, x], order=3, mode="nearest")


def directions(flat, sigma):
    """Direction of the streaks at every pixel, in degrees from the axis, and its weight."""
    rows, mixed, columns = structure_tensor(flat, sigma=sigma, order="rc")
    # The gradient stands across the streaks; turned by a right angle it runs along them.
    gradient = 0.5 * numpy.arctan2(2 * mixed, columns - rows)
    energy = rows + columns
    clear = numpy.hypot(rows - columns, 2 * mixed) / numpy.maximum(energy, 1e-12)
    edge = int(4 * sigma)
    inside = (slice(edge, -edge), slice(edge, -edge))
    return numpy.degrees(gradient + numpy.pi / 2)[inside].ravel(), (clear**2 * numpy.sqrt(energy))[inside].ravel()


def modes(degrees, weights, concentration=250):
    """The two strongest modes of a kernel estimate on the circle of directions, one on either side of the axis."""
    grid = numpy.arange(-90, 90, 0.1)
    bins, _ = numpy.histogram((degrees + 90) % 180 - 90, bins=numpy.arange(-90.05, 90, 0.1), weights=weights)
    kernel = numpy.exp(concentration * (numpy.cos(2 * numpy.radians(grid)) - 1))
    density = numpy.real(numpy.fft.ifft(numpy.fft.fft(bins) * numpy.fft.fft(numpy.fft.ifftshift(kernel))))
    found = []
    for side in (grid < -5) & (grid > -85), (grid > 5) & (grid < 85):
        at = numpy.flatnonzero(side)[numpy.argmax(density[side])]
        below, here, above = density[at - 1], density[at], density[at + 1]
        found.append(grid[at] + 0.05 * (below - above) / (below - 2 * here + above))
    return found


folder = pathlib.Path(sys.argv[1])
print(f"// scikit-image {skimage.__version__}, NumPy {numpy.__version__}")
for row in csv.DictReader((folder / "library.csv").open()):
    picture = numpy.asarray(Image.open(folder / f"{row['name']}.png").convert("L"), dtype=float) / 255
    sigma = max(1.0, float(row["thread"]) / 16)
    falling, rising = modes(*directions(laid_flat(picture, row), sigma))
    print(f'("{row["name"]}", {(rising - falling) / 2:.2f}),')
