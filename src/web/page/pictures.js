/// Pictures that the page shows: the maker's own file, where the browser can decode it, and those of the server.

/// {url, width, height} of a file, or null where this browser cannot show it (HEIC in most).
export async function localPicture(file) {
  const url = URL.createObjectURL(file);
  const image = new Image();
  image.src = url;
  try {
    await image.decode();
    return { url, width: image.naturalWidth, height: image.naturalHeight };
  } catch {
    URL.revokeObjectURL(url);
    return null;
  }
}

/// {url, width, height} of the JPEG that came in an answer, or null.
export function serverPicture(picture) {
  if (!picture?.jpeg_base64) return null;
  const bytes = Uint8Array.from(atob(picture.jpeg_base64), (letter) => letter.charCodeAt(0));
  return {
    url: URL.createObjectURL(new Blob([bytes], { type: 'image/jpeg' })),
    width: picture.width_px,
    height: picture.height_px,
  };
}

export function forget(picture) {
  if (picture) URL.revokeObjectURL(picture.url);
}

/// Size of the upright photo in its own pixels: as the answer says it, else as the browser decoded it. Null where neither
/// does.
export function photoSize(body, local) {
  const told = body?.report?.photo ?? body?.photo;
  if (told?.width_px) return { width: told.width_px, height: told.height_px };
  return local ? { width: local.width, height: local.height } : null;
}
