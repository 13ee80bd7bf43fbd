/// What can go wrong between the page and the server, as one kind of error.
///
/// kind: `lost` (no answer at all), `refused` (the program measured nothing and says why), `stopped` (by the maker),
/// otherwise the server's own code, as in `not-a-photo`. `refusal` and `picture` come with `refused`.
export class Trouble extends Error {
  constructor(
    kind,
    { message = '', hint = '', status = 0, refusal = null, picture = null, body = null, retryAfterS = 0 } = {},
  ) {
    super(message || kind);
    this.name = 'Trouble';
    Object.assign(this, { kind, hint, status, refusal, picture, body, retryAfterS });
  }
}

/// The trouble that an answer tells of. `body` is the parsed JSON, or null where it was none.
export function troubleOf(status, body, retryAfter = null) {
  if (body?.refusal) {
    const refusal = body.refusal.refusal ?? body.refusal;
    return new Trouble('refused', {
      status,
      refusal,
      body,
      message: refusal.message,
      hint: refusal.hint,
      picture: body.picture ?? null,
    });
  }
  const error = body?.error ?? {};
  const kind = error.code ?? byStatus[status] ?? 'server-fault';
  return new Trouble(kind, {
    status,
    message: error.message ?? '',
    hint: error.hint ?? '',
    retryAfterS: Number(retryAfter) || 0,
  });
}

const byStatus = {
  401: 'no-key',
  403: 'no-key',
  413: 'too-large',
  415: 'not-a-photo',
  429: 'busy',
  503: 'busy',
  504: 'too-slow',
};
