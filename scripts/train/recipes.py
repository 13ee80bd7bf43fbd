"""Which faces a fabric shows, row by row, and how tall its rows are."""
import torch

import stitches as st

# Row height over stitch width. Wider than published gauges on purpose: hands differ.
RATIO = {"sc": (0.70, 1.14), "sc-blo": (0.76, 1.18), "sc-flo": (0.76, 1.18), "hdc": (1.0, 1.62),
         "hdc-blo": (0.98, 1.5), "dc": (1.35, 2.3), "tr": (2.1, 3.1), "stockinette": (0.5, 1.02),
         "other": (0.55, 1.9)}
# Textured fabrics: garter, rib, tall and slip stitches, moss, raised posts, waffle, stitch and chain in turn,
# slip-stitch rows.
TEXTURED = 8
TURNED = (0, 2, 3, 5, 6, 7)  # those whose rows are always worked both ways
# Yarn radii in one stitch width.
THIN = {"stockinette": (3.5, 5.4), "dc": (4.0, 7.0), "tr": (4.0, 7.0), "hdc": (3.9, 6.8), "other": (3.8, 6.0)}
SAMPLES = {"dc": 22, "tr": 28, "hdc": 18, "hdc-blo": 18, "other": 20}
WEIGHT = {"sc": 0.19, "sc-blo": 0.11, "sc-flo": 0.06, "hdc": 0.16, "hdc-blo": 0.10, "dc": 0.13, "tr": 0.05,
          "stockinette": 0.11, "other": 0.09}


def face(family, back, c, other=0, worked="flat"):
    """Draw one face of the family into the cells; `other` chooses among the textured fabrics.

    Worked through the back loop, a row shows the free front loop of the row below along its foot where it
    faces us. Through the front loop the free loop lies on the far side: turned work shows it under the rows
    whose back faces us, work in rounds shows it deep in the gap between the rows."""
    if family == "sc":
        (st.single_back if back else st.single_front)(c)
    elif family == "sc-blo":
        if back:
            (st.single_back if chance(c, 0.7) else st.single_front)(c)
        else:
            st.single_front(c, c.draw(1.6, 3.6))
    elif family == "sc-flo":
        if back:
            st.single_back(c, c.draw(1.4, 3.2))
        else:
            if worked == "round":
                st.free_loop(c, c.draw(-1.6, -0.2))
            st.single_front(c)
    elif family == "hdc":
        half_double_any(c, back, None, 0.25 if worked == "flat" else 0.0)
    elif family == "hdc-blo":
        half_double_any(c, back, None if back else c.draw(1.6, 3.4), 0.0)
    elif family == "dc":
        st.post(c, 1 if chance(c, 0.75) else 2)
    elif family == "tr":
        st.post(c, 2 if chance(c, 0.7) else 3)
    elif family == "stockinette":
        (st.purl if other == 1 else st.knit)(c)
    else:
        textured(c, other, back)


def chance(c, of):
    """One coin for the whole batch of cells."""
    return bool(torch.rand(1, generator=c.coin).item() < of)


def half_double_any(c, back, ridge, third_loop):
    """Mostly its own face; tight work looks like a short tall stitch or a tall short one."""
    kind = float(torch.rand(1, generator=c.coin))
    if kind < 0.82:
        st.half_double(c, back, ridge, third_loop)
    elif kind < 0.92:
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
        wide = 1 if chance(c, 0.5) else 2
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
    elif other == 5:                                 # waffle: raised posts and raised rows around hollows
        first = (i % 3 == 0).float().expand(1, c.rows, c.columns)
        high, low = c.draw(1.2, 2.4), (c.draw(0.6, 1.8) if back else c.draw(-1.6, -0.4))
        c.shown = first
        st.post(c, 1, radius=1.15, lift=high)
        c.shown = 1 - first
        st.post(c, 1, radius=1.1 if back else 1.0, lift=low)
        c.shown = None
    elif other == 6:                                 # a stitch and a chain in turn, into the chains below
        first = ((i + (1 if back else 0)) % 2 == 0).float().expand(1, c.rows, c.columns)
        c.shown = first
        (st.single_back if back else st.single_front)(c)
        c.shown = 1 - first
        st.loops(c, c.draw(0.6, 0.95), c.draw(0.0, 1.4), c.draw(0.1, 0.3), c.sign())
        c.shown = None
    elif other == 7:                                 # slip stitches through one loop: flat chains side by side
        st.loops(c, c.draw(0.25, 0.5), c.draw(0.5, 1.6), c.draw(0.3, 0.5), c.sign(), c.draw(1.0, 1.3))
        if not back or chance(c, 0.5):
            st.free_loop(c, c.draw(0.6, 2.2))
    else:                                            # raised posts every second or third stitch
        first = (((i + j) if chance(c, 0.5) else i) % 3 == 0).float().expand(1, c.rows, c.columns)
        c.shown = first
        st.post(c, 2, radius=1.2)
        c.shown = 1 - first
        st.post(c, 1)
        c.shown = None
