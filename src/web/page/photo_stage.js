/// The photo in a frame that zooms and moves by fingers, wheel, buttons and keys, with room above it for handles.
import { button, make } from './dom.js';
import { fitted, kept, moved, placed, shown, toPhoto, toScreen, zoomed, zoomStep } from './photo_frame.js';
import { stageGestures } from './stage_gestures.js';
import { word } from './words.js';

const keyMovePx = 40;
const wheelPower = 0.0015;
const revealMarginPx = 48;
const unknown = { width: 4, height: 3 };

export function photoStage() {
  const image = make('img', { class: 'stage-picture', alt: '', draggable: 'false' });
  const sheet = make('div', { class: 'stage-sheet' }, image);
  const layer = make('div', { class: 'stage-layer' });
  const stage = make(
    'div',
    { class: 'stage', tabindex: '0', role: 'group', 'aria-label': word('photo.stage') },
    sheet,
    layer,
  );
  const zoomIn = button('+', () => zoom(zoomStep), { class: 'tool-button', 'aria-label': word('photo.in') });
  const zoomOut = button('−', () => zoom(1 / zoomStep), { class: 'tool-button', 'aria-label': word('photo.out') });
  const all = button(word('photo.all'), () => showAll(), {
    class: 'tool-button',
    'aria-label': word('photo.all-full'),
  });
  const bar = make('div', { class: 'stage-bar' }, zoomIn, zoomOut, all);
  const frame = make('div', { class: 'stage-frame' }, stage, bar, make('p', { class: 'quiet' }, word('photo.help')));
  let photo = unknown;
  let picture = null;
  let room = { width: 0, height: 0 };
  let view = fitted(photo, { width: 1, height: 1 });
  const viewers = new Set();
  let ontap = () => {};

  function setView(next) {
    view = next;
    sheet.style.transform = `translate(${view.x}px, ${view.y}px) scale(${view.scale})`;
    stage.classList.toggle('is-near', view.scale > fitted(photo, room).scale * 1.001);
    viewers.forEach((viewer) => viewer(view));
  }
  const middle = () => [room.width / 2, room.height / 2];
  const zoom = (factor, point = middle()) => setView(zoomed(view, factor, point, photo, room));
  const showAll = () => setView(fitted(photo, room));

  function lay() {
    sheet.style.width = `${photo.width}px`;
    sheet.style.height = `${photo.height}px`;
    stage.style.aspectRatio = `${photo.width} / ${photo.height}`;
    if (!picture) return;
    const { left, top, width, height } = placed(picture, photo);
    Object.assign(image.style, { left: `${left}px`, top: `${top}px`, width: `${width}px`, height: `${height}px` });
  }

  new ResizeObserver(() => {
    const whole = view.scale <= fitted(photo, room).scale * 1.001;
    room = { width: stage.clientWidth, height: stage.clientHeight };
    if (room.width > 0) setView(whole ? fitted(photo, room) : kept(view, photo, room));
  }).observe(stage);

  stageGestures(stage, {
    view: () => view,
    setView,
    photo: () => photo,
    room: () => room,
    ontap: (point) => ontap(toPhoto(view, point)),
  });

  stage.addEventListener(
    'wheel',
    (event) => {
      // The page scrolls under the wheel until the photo is chosen, by a click say.
      if (!event.ctrlKey && !stage.contains(document.activeElement)) return;
      event.preventDefault();
      const corner = stage.getBoundingClientRect();
      zoom(Math.exp(-event.deltaY * wheelPower), [event.clientX - corner.left, event.clientY - corner.top]);
    },
    { passive: false },
  );

  const keys = {
    '+': () => zoom(zoomStep),
    '=': () => zoom(zoomStep),
    '-': () => zoom(1 / zoomStep),
    0: showAll,
    ArrowLeft: () => setView(moved(view, [keyMovePx, 0], photo, room)),
    ArrowRight: () => setView(moved(view, [-keyMovePx, 0], photo, room)),
    ArrowUp: () => setView(moved(view, [0, keyMovePx], photo, room)),
    ArrowDown: () => setView(moved(view, [0, -keyMovePx], photo, room)),
  };
  stage.addEventListener('keydown', (event) => {
    const wholeInView = !stage.classList.contains('is-near');
    if (event.target !== stage || event.ctrlKey || event.metaKey || event.altKey) return;
    if (!(event.key in keys) || (wholeInView && event.key.startsWith('Arrow'))) return; // arrows scroll the page then
    event.preventDefault();
    keys[event.key]();
  });

  return {
    frame,
    stage,
    layer,
    bar,
    image,
    /// Shows a picture {url, width, height} of a photo {width, height}; the view stays where the photo is the same.
    show({ picture: nextPicture, photo: nextPhoto, alt, keep = true }) {
      const same = keep && nextPhoto.width === photo.width && nextPhoto.height === photo.height;
      photo = nextPhoto;
      picture = nextPicture;
      if (image.src !== picture.url) image.src = picture.url;
      image.alt = alt;
      lay();
      room = { width: stage.clientWidth, height: stage.clientHeight };
      if (room.width > 0) setView(same ? kept(view, photo, room) : fitted(photo, room));
    },
    /// Brings a point of the photo into view where it is too near the edge or outside.
    reveal(point) {
      setView(shown(view, point, Math.min(revealMarginPx, room.width / 4, room.height / 4), photo, room));
    },
    get view() {
      return view;
    },
    get photo() {
      return photo;
    },
    get place() {
      return picture && placed(picture, photo);
    },
    get room() {
      return room;
    },
    screenOf: (point) => toScreen(view, point),
    photoOf: (point) => toPhoto(view, point),
    onview: (viewer) => viewers.add(viewer),
    set ontap(listener) {
      ontap = listener;
    },
  };
}
