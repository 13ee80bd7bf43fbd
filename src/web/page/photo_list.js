/// The photos of one piece that are sent together: what may be added to them. No elements, no network.

const bytes = (photos) => photos.reduce((sum, { size }) => sum + size, 0);

/// The photos with `added` behind them, or those there were and why not: `{photos, complaint}`, where the complaint is
/// null, `{key: 'heavy', size, limit}` in bytes of all together or `{key: 'many', limit}`.
export function withPhotos(photos, added, limits = {}) {
  const all = [...photos, ...added];
  const size = bytes(all);
  if (limits.photos && all.length > limits.photos) return { photos, complaint: { key: 'many', limit: limits.photos } };
  if (limits.upload_bytes && size > limits.upload_bytes)
    return { photos, complaint: { key: 'heavy', size, limit: limits.upload_bytes } };
  return { photos: all, complaint: null };
}

export const withoutPhoto = (photos, index) => photos.filter((_, i) => i !== index);
