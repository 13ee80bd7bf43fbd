"""Which faces a fabric shows, row by row, and how tall its rows are."""
import torch

import stitches as st

# Row height over stitch width. Wider than published gauges on purpose: hands differ.
RATIO = {"sc": (0.70, 1.14), "sc-blo": (0.76, 1.18), "sc-flo": (0.76, 1.18), "hdc": (1.0, 1.62),
         "hdc-blo": (0.98, 1.5), "dc": (1.35, 2.3), "tr": (2.1, 3.1), "stockinette": (0.5, 1.02),
         "other": (0.55, 1.9)}
# Yarn radii in one stitch width.
THIN = {"stockinette": (3.5, 5.4), "dc": (4.0, 7.0), "tr": (4.0, 7.0), "hdc": (3.9, 6.8), "other": (3.8, 6.0)}
SAMPLES = {"dc": 22, "tr": 28, "hdc": 18, "hdc-blo": 18, "other": 20}
WEIGHT = {"sc": 0.22, "sc-blo": 0.12, "sc-flo": 0.03, "hdc": 0.15, "hdc-blo": 0.05, "dc": 0.15, "tr": 0.04,
          "stockinette": 0.15, "other": 0.09}


def ridge_height(c, low, high):
    return c.draw(low, high)


def face(family, back, c, other=0):
    """Draw one face of the family into the cells; `other` chooses among the textured fabrics."""
    if family == "sc":
        (st.single_back if back else st.single_front)(c)
    elif family in ("sc-blo", "sc-flo"):
        low, high = (1.6, 3.6) if family == "sc-blo" else (0.6, 2.4)
        ridge = None if back else ridge_height(c, low, high)
        if back and c_flip(c):
            st.single_back(c)
        else:
            st.single_front(c, ridge)
    elif family == "hdc":
        half_double_any(c, back, None)
    elif family == "hdc-blo":
        half_double_any(c, back, None if back else ridge_height(c, 1.6, 3.4))
    elif family == "dc":
        st.post(c, 1 if c_flip(c) else 2)
    elif family == "tr":
        st.post(c, 2 if c_flip(c) else 3)
    elif family == "stockinette":
        (st.purl if other == 1 else st.knit)(c)
    else:
        textured(c, other, back)


def c_flip(c):
    """One coin for the whole batch of cells."""
    return bool(torch.rand(1, generator=c.coin).item() < 0.5)


def half_double_any(c, back, ridge):
    kind = float(torch.rand(1, generator=c.coin))
    if kind < 0.5:
        st.half_double(c, back, ridge)
    elif kind < 0.75:
        st.post(c, 1, ridge, radius=c.draw(1.0, 1.25))
    else:
        (st.single_back if back else st.single_front)(c, ridge)


def textured(c, other, back):
    """Garter, rib, tall and short stitches in alternation, post stitches in relief."""
    i = torch.arange(c.columns, device=c.device)[None, None, :]
    j = torch.arange(c.rows, device=c.device)[None, :, None]
    if other == 0:                                   # garter: a ridge every second row
        if back:
            st.knit(c, lift=-1.6)
        else:
            st.purl(c, lift=0.8)
    elif other == 1:                                 # rib, one or two wide
        wide = 1 if c_flip(c) else 2
        first = ((i // wide) % 2 == 0).float()
        st.knit(c, shown=first.expand(1, c.rows, c.columns), lift=0.8)
        st.purl(c, shown=(1 - first).expand(1, c.rows, c.columns), lift=-1.0)
    elif other == 2:                                 # tall and slip stitches in alternation
        # the batch holds every second row, so the checker comes from `back`
        first = ((i + (1 if back else 0)) % 2 == 0).float().expand(1, c.rows, c.columns)
        c.shown = first
        st.post(c, 1)
        c.shown = 1 - first
        st.slip(c)
        c.shown = None
    elif other == 3:                                 # moss: knit and purl checkered
        first = ((i + (1 if back else 0)) % 2 == 0).float().expand(1, c.rows, c.columns)
        st.knit(c, shown=first)
        st.purl(c, shown=1 - first)
    else:                                            # raised posts every second or third stitch
        first = (((i + j) if c_flip(c) else i) % 3 == 0).float().expand(1, c.rows, c.columns)
        c.shown = first
        st.post(c, 2, radius=1.2)
        c.shown = 1 - first
        st.post(c, 1)
        c.shown = None
