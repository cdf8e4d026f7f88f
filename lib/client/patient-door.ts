/** Where a patient's doors are. */
export const patientDoor = (id: string) => `/api/patients/${encodeURIComponent(id)}`
