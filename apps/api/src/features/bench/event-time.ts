// Told the same way wherever something happened; the bench reads it under its own roof.
export { tellTime, type Told } from '#platform/told-time'
