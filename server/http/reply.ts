import type { ApiError, ApiErrorCode } from '../../lib/interchange/api.ts'

export interface Reply {
  readonly status: number
  /** bytes as they are, everything else as JSON */
  readonly body: unknown
  readonly headers?: Readonly<Record<string, string>>
}

export const ok = (body: unknown): Reply => ({ status: 200, body })
export const created = (body: unknown): Reply => ({ status: 201, body })

/** Status and sentence of each refusal: what happened, and what to do now. */
const refusals: { readonly [Code in ApiErrorCode]: { readonly status: number; readonly message: string } } = {
  'bad-request': { status: 400, message: 'The request does not have the form that is needed.' },
  'not-json': { status: 415, message: 'Send the request as JSON, with content-type application/json.' },
  'too-large': { status: 413, message: 'The request is too large; shorten the text and send it again.' },
  'cross-site': {
    status: 403,
    message: 'The request came from another site. Open the board at its own address and try again.',
  },
  'not-signed-in': { status: 401, message: 'Open the invitation link that you were sent to join.' },
  'not-permitted': {
    status: 403,
    message: 'Your invitation does not cover this. Ask whoever invited you for a link that does.',
  },
  'not-found': { status: 404, message: 'There is nothing at this address. Check it, or start from the list of cases.' },
  'method-not-allowed': { status: 405, message: 'This address does not take such a request.' },
  'link-unknown': {
    status: 404,
    message: 'This invitation link is not known. Check that the whole link was copied, or ask for a new one.',
  },
  'link-expired': { status: 410, message: 'This invitation link has expired. Ask whoever sent it for a new one.' },
  'link-revoked': { status: 410, message: 'This invitation link was withdrawn. Ask whoever sent it for a new one.' },
  'too-many-attempts': { status: 429, message: 'Too many links were tried from here. Wait ten minutes and try again.' },
  conflict: { status: 409, message: 'Somebody else changed this at the same time. Load the page again.' },
  'vote-closed': { status: 409, message: 'This vote is closed. A ballot cast before counts as it was.' },
  'too-many-requests': { status: 429, message: 'That were too many requests at once. Wait a few seconds and go on.' },
  'no-consent': {
    status: 409,
    message:
      'Consent to broadcasting is not recorded for this case. Record it in the details of the case, then bring it on.',
  },
  'edit-refused': { status: 409, message: 'This was not written.' },
  'picture-unknown-type': {
    status: 415,
    message: 'This is neither a PNG nor a JPEG picture. Save it as one of these and send it again.',
  },
  'picture-unsupported': {
    status: 422,
    message:
      'This sort of picture is not taken: it moves, is interlaced, or has colours for print. Save it as a plain JPEG and send it again.',
  },
  'picture-broken': {
    status: 422,
    message: 'This picture is damaged, cut short, or carries something behind its end. Take it anew or save it anew.',
  },
  'picture-too-large': {
    status: 413,
    message: 'A photograph has at most 1 MB and 4096 pixels a side. Make it smaller and send it again.',
  },
  'too-many-pictures': {
    status: 409,
    message: 'This case has as many photographs as a case may have. Withdraw one that is not needed.',
  },
  'bad-archive': { status: 422, message: 'This archive cannot be taken in.' },
  'case-taken': {
    status: 409,
    message:
      'There is, or was, a case of this id here. Nothing was changed. Take the archive in as a copy if it has to stand beside it.',
  },
  'case-erased': { status: 410, message: 'This case has been erased by the owner of this installation.' },
  'label-differs': { status: 409, message: 'What was typed is not the name of this case. Nothing was erased.' },
  'no-header': {
    status: 409,
    message: 'This case says nothing of its patient yet. Enter the details of the case, then export it.',
  },
  unavailable: { status: 503, message: 'The server cannot reach its data at the moment. Try again in a minute.' },
  internal: {
    status: 500,
    message: 'The server made a mistake. Try again; if it happens again, tell whoever runs it.',
  },
}

export function refuse(code: ApiErrorCode, detail?: string): Reply {
  const { status, message } = refusals[code]
  const body: ApiError = { error: { code, message: detail === undefined ? message : `${message} ${detail}` } }
  return { status, body }
}
